"""What lies ahead of a maker's line, as tables tell it: open days, past output, supply, plan, and the futures drawn from them."""
