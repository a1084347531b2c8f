package clinic.stimshelf.people;

import clinic.stimshelf.web.Option;
import java.util.List;
import java.util.stream.Stream;

/** What the forms of this room offer. */
final class Choices {
  private Choices() {}

  static final List<Option> LANGUAGES =
      List.of(
          new Option("en", "English"),
          new Option("es", "Spanish"),
          new Option("zh", "Chinese"),
          new Option("vi", "Vietnamese"),
          new Option("ko", "Korean"),
          new Option("ru", "Russian"),
          new Option("ar", "Arabic"),
          new Option("fr", "French"),
          new Option("pt", "Portuguese"),
          new Option("ht", "Haitian Creole"),
          new Option("pl", "Polish"),
          new Option("tl", "Tagalog"),
          new Option("de", "German"),
          new Option("so", "Somali"));

  static final List<Option> WAYS =
      Stream.of(ReachBy.values()).map(way -> new Option(way.word(), way.words())).toList();

  static final List<Option> SIDES =
      Stream.of(Side.values()).map(side -> new Option(side.word(), side.words("en"))).toList();

  static final List<Option> MEANS =
      List.of(new Option("paper", "on paper"), new Option("screen", "on the screen"));

  static final List<Option> CONSENTS =
      Stream.of(ConsentKind.values()).map(kind -> new Option(kind.word(), kind.words())).toList();

  /** The languages, and the one that stands there if it is another. */
  static List<Option> languagesWith(String tag) {
    return tag == null || LANGUAGES.stream().anyMatch(one -> one.value().equals(tag))
        ? LANGUAGES
        : Stream.concat(LANGUAGES.stream(), Stream.of(new Option(tag, tag))).toList();
  }

  static String language(String tag) {
    return LANGUAGES.stream()
        .filter(one -> one.value().equals(tag))
        .map(Option::words)
        .findFirst()
        .orElse(tag);
  }

  static List<Option> muscles(Muscles muscles) {
    return muscles.all().stream()
        .map(muscle -> new Option(muscle.key(), muscle.english()))
        .toList();
  }
}
