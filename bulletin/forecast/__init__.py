"""When the line will have made what is waiting: simulated output, windows read off it, and how often such windows came true."""
