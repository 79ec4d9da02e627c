"""What bulletins on record promised, held against what came."""
