import { linkToFiles } from "./folder.js";
import { keepForLater } from "./keep.js";
import { showAround } from "./show-around.js";

showAround();
linkToFiles();
void keepForLater();
