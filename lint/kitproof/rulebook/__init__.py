"""Rule files to checked rules: the expression language, its three outcomes, and what a house sets.

`load` is in `loading`, the rules in `rules`, what they say in `messages`, mistakes in `errors`, house settings in
`settings`. Nothing is imported here: an unchanged rule book is taken as it was kept, without the reading of rules.
"""
