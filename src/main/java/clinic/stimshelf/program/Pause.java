package clinic.stimshelf.program;

import clinic.stimshelf.calc.days.Span;
import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.FetchType;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.JoinColumn;
import jakarta.persistence.ManyToOne;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;
import java.time.Instant;
import java.time.LocalDate;

/** Days without sessions, both ends included. */
@Entity
@Table(name = "program_pause")
class Pause {
  @Id
  @SequenceGenerator(
      name = "program_pause_seq",
      sequenceName = "program_pause_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "program_pause_seq")
  Long id;

  @ManyToOne(fetch = FetchType.LAZY, optional = false)
  @JoinColumn(name = "program_id")
  Program program;

  @Column(name = "from_day")
  LocalDate fromDay;

  @Column(name = "to_day")
  LocalDate toDay;

  String reason;

  @Column(name = "entered_at")
  Instant enteredAt;

  boolean covers(LocalDate day) {
    return !day.isBefore(fromDay) && !day.isAfter(toDay);
  }

  ProgramView.PauseView view() {
    return new ProgramView.PauseView(id, fromDay, toDay, reason);
  }

  Span<LocalDate> span() {
    return Span.of(fromDay, toDay.plusDays(1));
  }
}
