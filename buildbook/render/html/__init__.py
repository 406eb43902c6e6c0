"""Pages by the templates of a theme, the maker's Markdown as HTML, the index as scripts."""
