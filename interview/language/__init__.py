"""What did the customer say? Words in, facts out; facts in, words out."""
