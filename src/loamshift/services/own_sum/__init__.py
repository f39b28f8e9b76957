"""What is the sum behind this number of this bed?"""
