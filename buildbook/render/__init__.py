"""Renderers: a page model in, text or bytes out. None writes a file, none sees a job.

photo.py   a photo -> upright sRGB copies at three sizes with no metadata
prose.py   the maker's Markdown -> safe HTML, with pictures that the model allows
colour.py  the colour of a wood -> pairs that are legible on paper and at night
drawing/   page models -> pictures as inline SVG
theme.py   a theme's folder -> templates; a model -> a page
figures.py Summary -> summary.json
"""
