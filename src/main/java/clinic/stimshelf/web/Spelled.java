package clinic.stimshelf.web;

import java.util.Arrays;
import java.util.function.Function;
import java.util.stream.Collectors;

/** Words that scripts, forms and files spell for one of a few values. */
public final class Spelled {
  private Spelled() {}

  /**
   * The value that is spelled so.
   *
   * @param what begins the sentence that is said otherwise, such as “The reason”
   * @throws IllegalArgumentException naming every word there is
   */
  public static <T> T one(String what, T[] all, Function<T, String> word, String wanted) {
    return Arrays.stream(all)
        .filter(one -> word.apply(one).equals(wanted))
        .findFirst()
        .orElseThrow(
            () ->
                new IllegalArgumentException(
                    what
                        + " is one of "
                        + Arrays.stream(all).map(word).collect(Collectors.joining(", "))
                        + "."));
  }
}
