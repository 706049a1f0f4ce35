import { counts, inVersion, perMove, type Rule } from "./rule.js";

export const rushed: Rule = {
  name: "rushed",
  severity: "warning",
  why: "More than one and a half turns in under a second, from standing to lying in under half a second, or a change of height on part of a count: bodies need longer. (Common practice, no source.)",
  good: counts("1-2: { do: Double turn to the right, turn: 2 right, risk: [spin] }\n3-8: hold"),
  bad: counts("1: { do: Double turn to the right, turn: 2 right, risk: [spin] }\n2-8: hold"),
  find: (scene) =>
    perMove(scene, (move, version) => {
      const seconds = move.end.sub(move.start).valueOf();
      const time = `${seconds.toFixed(1)} s${inVersion(scene, version)}`;
      if (Math.abs(move.turn) > 12 && seconds < 1)
        return `more than one and a half turns in ${time}; turn less, or give it more counts`;
      if (move.before.height === move.after.height) return undefined;
      if (move.before.height === "standing" && move.after.height === "lying" && seconds < 0.5)
        return `from standing to lying in ${time}; give it more counts`;
      if (move.length.lt(1))
        return `from ${move.before.height} to ${move.after.height} on part of a count${inVersion(scene, version)}; give the change of height a count of its own`;
      return undefined;
    }),
};
