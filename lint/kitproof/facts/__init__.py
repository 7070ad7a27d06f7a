"""Facts: named, typed, documented numbers and truths about a rig, a joint, a packed thing and the rest."""
