"""The bed as the decisions see it: soil, aim, water and climate."""
