package clinic.stimshelf.exchange;

/** A file as handed over. */
record SourceFile(String name, byte[] bytes) {

  /** The name without folder and ending, which says what the file holds. */
  String stem() {
    String last = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
    int dot = last.indexOf('.');
    return dot < 0 ? last : last.substring(0, dot);
  }
}
