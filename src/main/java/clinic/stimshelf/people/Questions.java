package clinic.stimshelf.people;

import clinic.stimshelf.web.ConfigFiles;
import io.quarkus.runtime.Startup;
import jakarta.inject.Inject;
import jakarta.inject.Singleton;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;

/** The screening questions of {@code config/screening.yaml}, in its order. */
@Startup
@Singleton
public class Questions {
  static final String FILE = "screening.yaml";
  private static final Pattern KEY = Pattern.compile("[a-z0-9_]{1,40}");

  private final Map<String, Question> questions = new LinkedHashMap<>();

  record Sheet(List<Question> questions) {}

  @Inject
  Questions(ConfigFiles files) {
    this(files.read(FILE, Sheet.class));
  }

  /**
   * @throws IllegalStateException naming everything that is wrong in the file
   */
  Questions(Sheet sheet) {
    List<String> faults = new ArrayList<>();
    if (sheet.questions() == null || sheet.questions().isEmpty()) {
      faults.add("It asks nothing.");
    } else {
      sheet.questions().forEach(question -> take(question, faults));
    }
    ConfigFiles.refuse(FILE, faults);
  }

  private void take(Question question, List<String> faults) {
    String name = "Question “" + question.key() + "”";
    if (question.key() == null || !KEY.matcher(question.key()).matches()) {
      faults.add(name + " needs a key of a-z, 0-9 and _.");
    }
    if (blank(question.ask())) {
      faults.add(name + " needs “ask”.");
    }
    if (blank(question.source())) {
      faults.add(name + " needs “source”: where it comes from, or that it has none.");
    }
    if (question.effect() == null) {
      faults.add(name + " needs an effect: contraindication, precaution, hold or information.");
    }
    if (question.region() == null || !regions().contains(question.region())) {
      faults.add(name + " needs a region: " + String.join(", ", regions()) + ".");
    }
    if (blank(question.patient()) != blank(question.patientSpanish())) {
      faults.add(name + " needs the patient's words in both languages, or in none.");
    }
    checkVariants(question, name, faults);
    if (questions.put(question.key(), question) != null) {
      faults.add(name + " stands there twice.");
    }
  }

  private static void checkVariants(Question question, String name, List<String> faults) {
    Question.Alternative alternative = question.alternative();
    if (alternative != null
        && (blank(alternative.answer())
            || alternative.effect() == null
            || question.effect() == null
            || alternative.effect().compareTo(question.effect()) > 0)) {
      faults.add(name + " needs an alternative with an answer and an effect that is no stronger.");
    }
    Question.Over over = question.over();
    if (over != null
        && (over.near() == null
            || !Muscles.PLACES.containsAll(over.near())
            || over.effect() == null)) {
      faults.add(name + " needs, under “over”, places in “near” and an effect.");
    }
    boolean holds =
        question.effect() == Effect.HOLD
            || question.atHome() == Effect.HOLD
            || (alternative != null && alternative.effect() == Effect.HOLD)
            || (over != null && over.effect() == Effect.HOLD);
    if (holds && blank(question.clearedBy())) {
      faults.add(name + " is a hold, so it must say under “cleared-by” who can clear it.");
    }
  }

  private static Set<String> regions() {
    Set<String> regions = new TreeSet<>(Muscles.PLACES);
    regions.addAll(List.of("any", "local", "limb"));
    return regions;
  }

  public Collection<Question> all() {
    return List.copyOf(questions.values());
  }

  public Optional<Question> find(String key) {
    return Optional.ofNullable(questions.get(key));
  }

  /** What is asked before this region is treated at home. */
  List<Question> askedFor(BodyRegion treated) {
    return questions.values().stream().filter(question -> question.asked(treated)).toList();
  }

  /** What the patient is asked; {@code null} where the region is not known yet. */
  List<Question> askedOfPatient(BodyRegion treated) {
    return questions.values().stream()
        .filter(question -> question.patient() != null)
        .filter(question -> treated == null || question.asked(treated))
        .toList();
  }

  private static boolean blank(String text) {
    return text == null || text.isBlank();
  }
}
