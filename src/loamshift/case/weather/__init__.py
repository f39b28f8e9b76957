"""Files of weather stations and soil thermometers, whatever their layout and units."""
