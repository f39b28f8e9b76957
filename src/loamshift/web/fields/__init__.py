"""Maps of fields: samples uploaded, zones with their rates, files to take along."""
