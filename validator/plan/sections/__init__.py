"""The sections of a plan, a module each; imported only when a plan has the section."""
