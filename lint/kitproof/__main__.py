"""`python -m kitproof` is the command."""

from kitproof.start import start

if __name__ == "__main__":
    start()
