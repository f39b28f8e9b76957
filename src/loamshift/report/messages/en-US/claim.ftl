### Where an American says something about a claim in other words.

claim-slow-on-top = On the surface it limes the top inch and works down slowly.
claim-at-the-surface = The top inch, where it lies, would fall to about pH { $lowest }.
