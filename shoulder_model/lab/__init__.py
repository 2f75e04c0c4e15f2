"""How the workbook is opened: JupyterLab on loopback, with settings of its own."""
