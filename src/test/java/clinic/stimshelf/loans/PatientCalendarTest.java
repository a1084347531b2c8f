package clinic.stimshelf.loans;

import static clinic.stimshelf.loans.LendingScene.get;
import static org.assertj.core.api.Assertions.assertThat;

import clinic.stimshelf.access.Credential;
import clinic.stimshelf.testing.Crew;
import clinic.stimshelf.web.Roles;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.StringReader;
import java.util.List;
import net.fortuna.ical4j.data.CalendarBuilder;
import net.fortuna.ical4j.model.Component;
import org.junit.jupiter.api.Test;

/** The calendar file that staff hand to a patient. */
@QuarkusTest
class PatientCalendarTest {
  @Inject LendingScene lending;
  @Inject Crew crew;

  @Test
  void itHoldsTheReturnDayUntilTheUnitIsBackAndNoWordOfTreatment() throws Exception {
    LendingScene.Scene clinic = lending.open();
    String unit = lending.unit(clinic);
    String loan = lending.lent(clinic, lending.signed(clinic), unit);
    String patient = get(clinic.desk(), "/api/loans/" + loan).extract().path("patientId");
    String file =
        get(clinic.desk(), "/patients/" + patient + "/calendar.ics")
            .statusCode(200)
            .contentType("text/calendar;charset=UTF-8")
            .extract()
            .asString();
    List<? extends Component> events =
        new CalendarBuilder().build(new StringReader(file)).getComponents(Component.VEVENT);
    assertThat(events).hasSize(1);
    assertThat(value(events.get(0), "DTSTART")).isEqualTo("20260415");
    assertThat(value(events.get(0), "SUMMARY")).isEqualTo("Return day");
    assertThat(value(events.get(0), "DESCRIPTION")).isEqualTo("Open 8:00 AM to 6:00 PM");
    assertThat(file).doesNotContain("Lindqvist", unit, "quadriceps", "stimul");
    Crew.Member elsewhere =
        crew.member(Roles.FRONT_DESK, Credential.NONE, crew.location(Crew.unique("else")));
    get(elsewhere, "/patients/" + patient + "/calendar.ics").statusCode(404);
  }

  private static String value(Component event, String name) {
    return event.getProperty(name).orElseThrow().getValue();
  }
}
