plan-retest-lab = Test again on { $days }: have a lab do it, and keep to that depth and method from then on.
