"""The unfolded example redone by hand: from the numbers printed in its report and nothing else."""
