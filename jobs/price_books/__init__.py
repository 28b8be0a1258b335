"""What the firm can buy, what its time costs and how it prices."""
