"""How the site is run: settings, first run, health, worker, backups. It knows nothing of lofts."""
