"""Pictures as SVG text, each with a table that says the same.

Pure: numbers and words that are made already in, text out. A file a picture, and `marks` that all
are drawn with: no style attribute and no script, so that a strict page takes them as they are.
"""
