"""The workbench: pages and JSON over the same services as the command line."""
