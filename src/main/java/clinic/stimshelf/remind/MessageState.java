package clinic.stimshelf.remind;

/** Where a message stands. */
enum MessageState {
  WAITING,
  /** Somebody is just sending it. */
  CLAIMED,
  SENT,
  FAILED,
  /** There is no server to send it with; people see it on a page. */
  UNSENT,
  CANCELLED
}
