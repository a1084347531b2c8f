package clinic.stimshelf.remind;

/** Why an address is not written to any more. */
enum StopReason {
  REFUSED("the address was refused"),
  BOUNCED("mail came back"),
  OPTED_OUT("the patient wants no more of them"),
  WRONG("it is somebody else's number");

  private final String words;

  StopReason(String words) {
    this.words = words;
  }

  String words() {
    return words;
  }
}
