"""Second devices: let one join with a code, see who has joined, trust the certificate."""
