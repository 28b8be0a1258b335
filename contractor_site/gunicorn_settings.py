"""gunicorn as measured for a small firm: `gunicorn -c python:contractor_site.gunicorn_settings`."""

from __future__ import annotations

wsgi_app = "contractor_site.wsgi"
bind = "127.0.0.1:8000"
workers = 2
threads = 4
worker_class = "gthread"
timeout = 60
graceful_timeout = 30
# Making a PDF leaves a third of a megabyte behind: start a worker afresh now and then, never both together.
max_requests = 2000
max_requests_jitter = 400
control_socket_disable = True  # systemd stops and restarts it; a socket in the home folder is one more door
accesslog = None  # the site logs its requests itself, without paths: a customer's link is a path
