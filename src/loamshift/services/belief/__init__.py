"""What could lie behind what is known: possible beds and how the column runs them."""
