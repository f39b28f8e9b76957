"""Which question first, and what must be asked before it can be answered?"""
