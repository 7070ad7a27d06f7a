"""`python -m kitproof` is the command."""

from kitproof.command import main

if __name__ == "__main__":
    main(prog_name="kitproof")
