"""What is changed in a list's text: its layout, and what a finding says to do, proved by proofing the changed list."""
