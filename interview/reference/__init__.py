"""What do the standards say? Tables with their sources, and typed loaders."""
