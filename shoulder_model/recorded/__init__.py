"""Panels without a kernel: every state of a declared grid recorded from the real panel, and looked up by a small script."""
