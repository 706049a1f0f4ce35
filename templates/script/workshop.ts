import { linkToFiles } from "./folder.js";
import { keepForLater } from "./keep.js";

linkToFiles();
void keepForLater();
