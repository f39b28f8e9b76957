"""How good are our forecasts: of a bed, a client, an office."""
