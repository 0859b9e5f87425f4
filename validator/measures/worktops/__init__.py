"""Worktops: their pieces, spans, overhangs, joints, cut-outs and care, and what is cut from which board."""
