"""Data: case files in and out, changes and their undoing, backups, and a client who leaves."""
