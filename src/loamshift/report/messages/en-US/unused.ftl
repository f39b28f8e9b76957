### Facts without influence, where an American says it in other words.

unused-carbonate-given = Given but not used: { $facts }. The free lime that the lab measured is used instead.
unused-scale-no-equation = The { $fact } is not used: we found no source for the equation of this method. The lab's own lime figure can be used instead.
