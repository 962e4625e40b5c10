"""What the record says of the loads, whatever the pair: what to mind, and the reactions of the shaft."""
