"""The one door of the service: what every request and every reply go through, written once as WSGI."""
