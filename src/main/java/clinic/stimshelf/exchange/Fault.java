package clinic.stimshelf.exchange;

/**
 * What is wrong in a file.
 *
 * @param file name of the file
 * @param line line in it, counted from 1 as an editor does; 0 where it is about the whole file
 * @param column its name in the header, empty where it is about the whole line
 * @param value what stands there
 * @param says what is wrong and what is allowed
 */
public record Fault(String file, long line, String column, String value, String says) {

  /** Everything in one line. */
  public String words() {
    StringBuilder words = new StringBuilder(file);
    if (line > 0) {
      words.append(", line ").append(line);
    }
    if (!column.isEmpty()) {
      words.append(", ").append(column);
    }
    if (!value.isEmpty()) {
      words.append(", “").append(value).append("”");
    }
    return words.append(": ").append(says).toString();
  }
}
