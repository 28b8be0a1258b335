"""What happens before Django can be imported: standard library only, so that bare Python is enough."""
