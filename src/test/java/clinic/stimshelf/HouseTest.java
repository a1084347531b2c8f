package clinic.stimshelf;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.methods;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;

import clinic.stimshelf.web.Idempotent;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import jakarta.ws.rs.POST;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.ZonedDateTime;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The house: a room may use only the rooms above it. */
class HouseTest {
  private static final String HOUSE = "clinic.stimshelf";

  /** From the top of the house down. */
  private static final List<String> ROOMS =
      List.of(
          "calc",
          "codes",
          "web",
          "audit",
          "location",
          "access",
          "people",
          "shelf",
          "pads",
          "program",
          "outcomes",
          "appointments",
          "loans",
          "remind",
          "recall",
          "desk",
          "link",
          "review",
          "whatif",
          "exchange");

  private static final JavaClasses ALL =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages(HOUSE);

  @TestFactory
  List<DynamicTest> a_room_uses_only_rooms_above_it() {
    return ROOMS.stream()
        .map(
            room ->
                DynamicTest.dynamicTest(
                    room,
                    () -> {
                      String[] below =
                          ROOMS.subList(ROOMS.indexOf(room) + 1, ROOMS.size()).stream()
                              .map(lower -> HOUSE + "." + lower + "..")
                              .toArray(String[]::new);
                      if (below.length > 0) {
                        noClasses()
                            .that()
                            .resideInAPackage(HOUSE + "." + room + "..")
                            .should()
                            .dependOnClassesThat()
                            .resideInAnyPackage(below)
                            .allowEmptyShould(true)
                            .check(ALL);
                      }
                    }))
        .toList();
  }

  @Test
  void every_class_lives_in_a_room() {
    String[] rooms = ROOMS.stream().map(room -> HOUSE + "." + room + "..").toArray(String[]::new);
    classes()
        .that()
        .haveSimpleNameNotEndingWith("package-info")
        .should()
        .resideInAnyPackage(rooms)
        .check(ALL);
  }

  /** So that the tests of roles and headers find every one of them. */
  @Test
  void what_answers_calls_is_named_pages_or_api() {
    classes()
        .that()
        .areAnnotatedWith(jakarta.ws.rs.Path.class)
        .should()
        .haveSimpleNameEndingWith("Pages")
        .orShould()
        .haveSimpleNameEndingWith("Api")
        .check(ALL);
  }

  @Test
  void rooms_form_no_cycle() {
    slices().matching(HOUSE + ".(*)..").should().beFreeOfCycles().check(ALL);
  }

  @Test
  void calc_and_codes_know_only_the_jdk_mathematics_and_barcodes() {
    classes()
        .that()
        .resideInAnyPackage(HOUSE + ".calc..", HOUSE + ".codes..")
        .should()
        .onlyDependOnClassesThat()
        .resideInAnyPackage(
            HOUSE + ".calc..",
            HOUSE + ".codes..",
            "java..",
            "org.jspecify..",
            "org.apache.commons.statistics..",
            "org.apache.commons.numbers..",
            "org.apache.commons.rng..",
            "org.hipparchus..",
            "org.jgrapht..",
            "uk.org.okapibarcode..")
        .check(ALL);
  }

  @Test
  void time_is_read_from_the_injected_clock() {
    for (Class<?> type : List.of(Instant.class, LocalDate.class, LocalDateTime.class)) {
      noClasses().should().callMethod(type, "now").check(ALL);
    }
    noClasses().should().callMethod(ZonedDateTime.class, "now").check(ALL);
    noClasses()
        .that()
        .doNotHaveSimpleName("SystemClock")
        .should()
        .callMethod(Clock.class, "systemUTC")
        .orShould()
        .callMethod(Clock.class, "systemDefaultZone")
        .check(ALL);
  }

  @Test
  void chance_is_injected() {
    noClasses().should().callConstructor(Random.class).check(ALL);
    noClasses().should().callMethod(Math.class, "random").check(ALL);
  }

  /** Except where the answer holds a secret, which is not kept, or nothing changes. */
  @Test
  void a_call_that_changes_something_can_be_repeated_under_its_key() {
    methods()
        .that()
        .areAnnotatedWith(POST.class)
        .and()
        .areDeclaredInClassesThat()
        .haveSimpleNameEndingWith("Api")
        .and()
        .areDeclaredInClassesThat()
        .resideOutsideOfPackages(
            HOUSE + ".access..", HOUSE + ".whatif..", HOUSE + ".exchange..", HOUSE + ".desk..")
        .should()
        .beAnnotatedWith(Idempotent.class)
        .check(ALL);
  }
}
