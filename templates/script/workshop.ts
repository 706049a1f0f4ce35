import { linkToFiles } from "./folder.js";
import { keepForLater } from "./keep.js";

linkToFiles();
keepForLater([]);
