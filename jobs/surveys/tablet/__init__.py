"""Surveys that were filled without a signal: what tablets carry out, and what they send in later."""
