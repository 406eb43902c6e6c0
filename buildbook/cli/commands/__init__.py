"""The commands, a module each: takes its options, does its work, says what came of it, and gives the exit code.

One is loaded only when it is asked for: most of what the program can do is not needed for the rest.
"""
