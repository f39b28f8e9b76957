"""The workbench for programs: JSON in and out under ``/api/v1/``, described by OpenAPI."""
