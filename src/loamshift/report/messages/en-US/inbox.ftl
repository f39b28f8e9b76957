### American wording of the reply to a question.

inbox-danger = { $danger ->
    [hurt] If anybody, or any animal, has swallowed it, breathed it in or has it in their eyes, get help at once: call Poison Control (1-800-222-1222), or 911 in an emergency; for an animal, call a veterinarian. Rinse eyes and skin with plenty of clean water for at least { $minutes } minutes. Keep the package to show.
    [caustic] Burnt and hydrated lime, strong acids and bleach burn eyes and skin. Do not open, spread or mix them until you have heard from us. Never mix bleach with an acid, and never pour water into an acid.
    [stop] Put nothing more on this bed for now, neither more of the product nor anything meant to undo it. Sweep up and keep what still lies dry on the surface.
   *[near] Keep children and animals off the bed, and away from the packages, until you have heard from us.
}
