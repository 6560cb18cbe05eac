/** What a difficulty means wherever it stands beside one of another version. */
export const difficultyScale =
  "Difficulty of the hardest bar at this tempo, each hand on its own staff: 0 is a rest, up to 50 it is comfortable, from 67 on it cannot be done.";
