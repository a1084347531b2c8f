package clinic.stimshelf.remind;

/** Where a reminder stands. */
enum ReminderState {
  WAITING,
  SENT,
  FAILED,
  DONE,
  CANCELLED
}
