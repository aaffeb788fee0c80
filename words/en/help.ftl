# Help of the command line; its English stands with the arguments.
