"""Letters: laid out for pages, sent and reopened, and the cards and sheets on paper."""
