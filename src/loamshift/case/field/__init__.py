"""Files of fields: samples and zones with their places, boundaries, and rates for a spreader."""
