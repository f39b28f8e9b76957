"""How did the year go, and what does the next one need?"""
