"""What several frame shapes share: finding frames of fixed length, layouts, patterns, numbers.

Everything here is as pure as the shapes themselves, and knows none of them. Being a
package, it is not taken for a shape.
"""
