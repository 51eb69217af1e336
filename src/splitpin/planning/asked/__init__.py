"""What a job asks: templates, roles and reports to tasks on components, or to what is to be done at once."""
