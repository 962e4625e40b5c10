"""The record as a whole: computed again, and held against another one."""
