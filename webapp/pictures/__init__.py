"""Drawings of every kind of animal, made while the page is made: plain Python in, SVG out."""
