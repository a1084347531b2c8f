package clinic.stimshelf.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;

/**
 * Against the federal holidays of 5 U.S.C. 6103 as the Office of Personnel Management lists them
 * (checks/10_us_federal_holidays.csv, column observed_date_mon_fri_schedule).
 */
class HolidaysTest {

  @Test
  void proposesEveryFederalHolidayOnTheDayOfficesClose() throws IOException {
    List<LocalDate> official =
        Files.readAllLines(Path.of("src/test/resources/checks/10_us_federal_holidays.csv")).stream()
            .skip(1)
            .map(line -> line.replaceAll("\"[^\"]*\"", "quoted").split(",")[4])
            .map(LocalDate::parse)
            .toList();
    assertThat(official).hasSizeGreaterThan(10);
    int first = official.stream().mapToInt(LocalDate::getYear).min().orElseThrow();
    int last = official.stream().mapToInt(LocalDate::getYear).max().orElseThrow();
    List<LocalDate> proposed =
        new Holidays()
            .between(LocalDate.of(first, 1, 1), LocalDate.of(last, 12, 31)).stream()
                .map(Holidays.Proposed::day)
                .collect(Collectors.toList());
    assertThat(proposed).containsExactlyElementsOf(official);
  }
}
