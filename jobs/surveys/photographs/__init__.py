"""Photographs: taken in, made anonymous, kept, and shown to people of the firm alone."""
