"""The workbook as a folder of files for any web server: Python runs in the reader's browser, nothing is installed.

``python -m shoulder_model site FOLDER`` builds it (`build`):

    parts.toml ──> download ──> distribution ──> compiling ──┐
    chapters, figures ──> chapters ───────────────────────────┼──> build (JupyterLite) ──> the folder
    figures of the panels without Python, measured times ─> start_page ┘

What the package itself does in such a page stands in `shoulder_model.in_page`.
"""
