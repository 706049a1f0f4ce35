import { showAround } from "./show-around.js";

showAround();
