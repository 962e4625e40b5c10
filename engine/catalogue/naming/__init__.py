"""The numberings in which a bearing may be named, one a module, and what a reading of a name fixes."""
