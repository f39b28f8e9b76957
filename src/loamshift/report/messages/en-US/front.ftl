headline-elsewhere-pot = { $count ->
    [one] Do not try to change the mix in { $these }; repot in fresh potting mix.
   *[other] Do not try to change the mix in { $these }; repot them in fresh potting mix.
}
