// Loaded before the command: goes on as a user who may write nowhere but where everybody may. Root is asked for no permission.
if (process.getuid?.() === 0) {
  process.setgroups([]);
  process.setgid(65534);
  process.setuid(65534);
}
