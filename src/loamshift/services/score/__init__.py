"""How good are our forecasts? Each issued one against the reading that followed it."""
