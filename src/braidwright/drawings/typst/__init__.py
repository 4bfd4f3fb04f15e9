"""The Typst sources of the pages, kept beside the code that feeds them."""
