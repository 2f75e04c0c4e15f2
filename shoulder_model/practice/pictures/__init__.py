"""The pictures that items ask about, made of `document.scene` shapes: a file for each thing that is shown."""
