"""What stages show, and the pages are made of: shapes of codes and numbers, and what many share.

A function here reads the state and words it; it computes no lean, no advice and no verdict.
"""
