"""What is sent to suppliers."""
