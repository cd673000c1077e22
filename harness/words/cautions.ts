/** What can hurt somebody, and the usual care; printed before a drive and in every report. */
export const CAUTIONS: readonly string[] = [
  'First try every new build with the driven wheels off the ground and fingers, hair and sleeves ' +
    'clear of wheels and gears.',
  'A model at 5 m/s injures feet and eyes: keep bystanders out of its reach, and children and ' +
    'pets off the floor it drives on.',
  'Keep a switch or plug within reach that cuts motor power whatever the hub does; ' +
    'software is no emergency stop.',
  'Lithium cells burn when shorted, crushed, overcharged or run flat: charge them watched, on a ' +
    'surface that does not burn, with a charger made for them.',
  'Motors and bridges get hot enough to burn skin and to soften plastic gears; ' +
    'let them cool before you touch them.',
  "Local rules, the venue's rules and licensed practice come before anything written here; this " +
    'tool gives no guarantee of safety.',
];
