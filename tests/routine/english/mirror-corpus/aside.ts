/**
 * The part of the mirror corpus that was kept aside while the rules were written: every third cue, in order.
 * It measures the rules and is not to be looked at to improve them. The same hand wrote the cues and the rules, so the
 * measure is kinder than a stranger's cues would be. Each line is a cue and its mirror.
 */
export const aside: Readonly<Record<string, readonly (readonly [cue: string, mirror: string])[]>> = {
  jazz: [
    ["Hit the pose right on the beat", "Hit the pose right on the beat"],
    [
      "Layout on the left leg, right arm reaching to the back corner",
      "Layout on the right leg, left arm reaching to the back corner",
    ],
    ["Turn left after the hit", "Turn right after the hit"],
    ["Pivot 1/2 to the left and snap with the right hand", "Pivot 1/2 to the right and snap with the left hand"],
    [
      "Fan kick outside, right leg high, and land right where you began",
      "Fan kick outside, left leg high, and land right where you began",
    ],
    ["Find the right height for the kick, your own", "Find the right height for the kick, your own"],
    ["Jazz hands right, jazz hands left, both hands up", "Jazz hands left, jazz hands right, both hands up"],
    ["Contract and look right, release and look left", "Contract and look left, release and look right"],
  ],
  ballet: [
    [
      "Make sure that the hips are at the right angle to the barre",
      "Make sure that the hips are at the right angle to the barre",
    ],
    [
      "Pirouette en dehors to the right from fourth, left foot in front",
      "Pirouette en dehors to the left from fourth, right foot in front",
    ],
    [
      "Soutenu turn to the left, finish croisé with the right foot front",
      "Soutenu turn to the right, finish croisé with the left foot front",
    ],
    ["Balancé right, balancé left, tombé pas de bourrée", "Balancé left, balancé right, tombé pas de bourrée"],
    ["Left-hand barre first, then the right-hand barre", "Right-hand barre first, then the left-hand barre"],
    ["Échappé, close right foot back", "Échappé, close left foot back"],
    ["Grand battement à la seconde, L leg, 3 times", "Grand battement à la seconde, R leg, 3 times"],
    ["Pas de chat travelling left, right foot leads", "Pas de chat travelling right, left foot leads"],
  ],
  ballroom: [
    ["Lead with the left hand, her right", "Lead with the right hand, her left"],
    ["Heel turn on RF, closing LF, right into the hover", "Heel turn on LF, closing RF, right into the hover"],
    ["Chassé to the right: side, close, side (RLR)", "Chassé to the left: side, close, side (LRL)"],
    ["Underarm turn to the right, lady on counts 2 and 3", "Underarm turn to the left, lady on counts 2 and 3"],
    ["Outside partner on his left-hand side", "Outside partner on his right-hand side"],
    [
      "Fallaway, then slip pivot to the left, about a quarter",
      "Fallaway, then slip pivot to the right, about a quarter",
    ],
  ],
  "line dance": [
    ["1/4 turn L stepping forward on L", "1/4 turn R stepping forward on R"],
    ["Pivot ½ left, weight to left", "Pivot ½ right, weight to right"],
    ["Sailor ¼ turn right, finish at 3 o'clock", "Sailor ¼ turn left, finish at 9 o'clock"],
    ["Stomp right, stomp left, clap right on 8", "Stomp left, stomp right, clap right on 8"],
    ["Rumba box: side left, together, forward left, hold", "Rumba box: side right, together, forward right, hold"],
    ["Hip bumps R, R, L, L", "Hip bumps L, L, R, R"],
    ["Paddle turn 1/8 left, four times, right foot pushing", "Paddle turn 1/8 right, four times, left foot pushing"],
    [
      "K-step: right forward diagonal, touch left, left back to centre, touch right",
      "K-step: left forward diagonal, touch right, right back to centre, touch left",
    ],
  ],
  "hip hop": [
    ["Bounce right, bounce left, rock it back", "Bounce left, bounce right, rock it back"],
    ["Groove low, lean left on 1, right on 3", "Groove low, lean right on 1, left on 3"],
    ["Top rock: step left, cross, step right, cross", "Top rock: step right, cross, step left, cross"],
    ["Six-step going clockwise, left leg through first", "Six-step going anticlockwise, right leg through first"],
    ["Look left like you left something there", "Look right like you left something there"],
    ["Skate step, R-L-R, then kick out L", "Skate step, L-R-L, then kick out R"],
    ["Running man, right leg first, eight times", "Running man, left leg first, eight times"],
    ["Two left, two right, clap", "Two right, two left, clap"],
  ],
  heels: [
    ["Hip to the right, hand slides down the left thigh", "Hip to the left, hand slides down the right thigh"],
    ["Sit into the left hip, right knee turned in", "Sit into the right hip, left knee turned in"],
    ["Down to the right knee, pads on", "Down to the left knee, pads on"],
    ["Spin on the left ball, right leg wraps", "Spin on the right ball, left leg wraps"],
    ["Choose the right shoes for this one", "Choose the right shoes for this one"],
    ["Arch, right hand behind the head", "Arch, left hand behind the head"],
  ],
  "contemporary floorwork": [
    ["Roll over the left shoulder to the belly", "Roll over the right shoulder to the belly"],
    ["Spiral to the left until the right hip lifts", "Spiral to the right until the left hip lifts"],
    [
      "Swing the right leg back, and you are right back where you started",
      "Swing the left leg back, and you are right back where you started",
    ],
    ["Lean into an unseen wall, left palm flat against it", "Lean into an unseen wall, right palm flat against it"],
    ["Left knee, right knee, hands, belly", "Right knee, left knee, hands, belly"],
    ["Breathe in right as the piano starts", "Breathe in right as the piano starts"],
    ["Reach to your left, right arm long", "Reach to your right, left arm long"],
    ["Turn the gaze right, the body left", "Turn the gaze left, the body right"],
  ],
  tap: [
    ["Flap R, flap L, flap heel R", "Flap L, flap R, flap heel L"],
    ["Every sound right in the pocket", "Every sound right in the pocket"],
    ["Drawback L, drawback R, stamp", "Drawback R, drawback L, stamp"],
    ['The accent is right on the "and"', 'The accent is right on the "and"'],
    ["Hop right, shuffle left, hop right, step left", "Hop left, shuffle right, hop left, step right"],
    ["Three lefts and a right", "Three rights and a left"],
  ],
  folk: [
    ["Left-hand star, halfway round", "Right-hand star, halfway round"],
    ["Grapevine to the left, hop on the right", "Grapevine to the right, hop on the left"],
    ["Right elbow turn, left elbow back", "Left elbow turn, right elbow back"],
    [
      "If a dancer is left without a partner, join the middle",
      "If a dancer is left without a partner, join the middle",
    ],
    ["Step-hop left, swing the right leg across", "Step-hop right, swing the left leg across"],
  ],
  chair: [
    ["Sit tall, right hand on the seat", "Sit tall, left hand on the seat"],
    ["Cross the right ankle over the left knee", "Cross the left ankle over the right knee"],
    ["Tip back, left foot stays on the floor", "Tip back, right foot stays on the floor"],
    ["Turn the chair with the feet, a quarter right", "Turn the chair with the feet, a quarter left"],
    ["Stretch to the right, look to the left", "Stretch to the left, look to the right"],
  ],
  acro: [
    ["Kick up on the left leg, hips right over the hands", "Kick up on the right leg, hips right over the hands"],
    ["Round-off left, rebound straight up", "Round-off right, rebound straight up"],
    ["Split, right leg front, hands by the hips", "Split, left leg front, hands by the hips"],
    ["Hold the handstand until you get it right", "Hold the handstand until you get it right"],
  ],
  "social partner dance": [
    ["Leader: left foot back, right foot in place", "Leader: right foot back, left foot in place"],
    ["Rock step, triple left, triple right", "Rock step, triple right, triple left"],
    ["Come right back into closed position", "Come right back into closed position"],
    ["Hammerlock: L arm high, R arm behind her back", "Hammerlock: R arm high, L arm behind her back"],
    ["Sugar push, ending left foot free", "Sugar push, ending right foot free"],
  ],
  "commercial and stage": [
    ["Enter downstage right, cross upstage left", "Enter downstage left, cross upstage right"],
    ["End in a clump, DSL", "End in a clump, DSR"],
    [
      "Front line peels off to the left, back line to the right",
      "Front line peels off to the right, back line to the left",
    ],
    ["Step to the R. Then drag to the L.", "Step to the L. Then drag to the R."],
    ["Hold until the lights have left you", "Hold until the lights have left you"],
    ["Leftmost dancer starts, everyone else freezes", "Rightmost dancer starts, everyone else freezes"],
    ["Diagonal run to the left back corner", "Diagonal run to the right back corner"],
  ],
};
