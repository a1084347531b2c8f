package clinic.stimshelf.audit;

import clinic.stimshelf.web.Page;
import clinic.stimshelf.web.Paging;
import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.panache.common.Parameters;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import jakarta.transaction.Transactional;
import java.time.Clock;
import java.time.Instant;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** The append-only trail: who did what to what, when, and what it was before and after. */
@ApplicationScoped
public class Trail {
  @Inject AuditEntries entries;

  @Inject Actor actor;

  @Inject Clock clock;

  @Inject ObjectMapper json;

  /**
   * Adds a line in the transaction of the change it tells of.
   *
   * @param before the thing, or the fields that change, as they were; {@code null} if it is new
   * @param after the same as they are now; {@code null} if nothing is left
   */
  @Transactional(Transactional.TxType.MANDATORY)
  public void record(
      Subject subject, String action, Happened happened, Object before, Object after) {
    record(subject, null, action, happened, before, after);
  }

  /** The same for something that took place at a location. */
  @Transactional(Transactional.TxType.MANDATORY)
  public void record(
      Subject subject,
      Long locationId,
      String action,
      Happened happened,
      Object before,
      Object after) {
    AuditEntry entry = new AuditEntry();
    entry.happenedAt = happened.at();
    entry.recordedAt = clock.instant();
    entry.staffId = actor.staffId();
    entry.actorName = actor.name();
    entry.subjectKind = subject.kind();
    entry.subjectId = subject.id();
    entry.locationId = locationId;
    entry.action = action;
    entry.lateReason = happened.lateReason();
    entry.beforeJson = write(before);
    entry.afterJson = write(after);
    entries.persist(entry);
  }

  /**
   * When something was last recorded about each of many subjects of a kind; what has no line is
   * left out.
   */
  @Transactional
  public Map<String, Instant> lastRecorded(String kind, Collection<String> ids) {
    Map<String, Instant> last = new HashMap<>();
    if (!ids.isEmpty()) {
      entries
          .getEntityManager()
          .createQuery(
              "select e.subjectId, max(e.recordedAt) from AuditEntry e where e.subjectKind = :kind"
                  + " and e.subjectId in :ids group by e.subjectId",
              Object[].class)
          .setParameter("kind", kind)
          .setParameter("ids", ids)
          .getResultList()
          .forEach(row -> last.put((String) row[0], (Instant) row[1]));
    }
    return last;
  }

  /** Everything about one subject, newest first, at most 500 lines. */
  @Transactional
  public List<TrailEntry> of(Subject subject) {
    return entries
        .find(
            "subjectKind = :kind and subjectId = :id order by happenedAt desc, id desc",
            Parameters.with("kind", subject.kind()).and("id", subject.id()))
        .page(0, 500)
        .stream()
        .map(this::read)
        .toList();
  }

  /** The trail, newest first; {@code subject} may name a kind alone, or be {@code null} for all. */
  @Transactional
  public Page<TrailEntry> search(Subject subject, Paging paging) {
    String where = "1 = 1";
    Parameters values = new Parameters();
    if (subject != null) {
      where = "subjectKind = :kind";
      values.and("kind", subject.kind());
      if (!subject.id().isEmpty()) {
        where += " and subjectId = :id";
        values.and("id", subject.id());
      }
    }
    List<TrailEntry> items =
        entries
            .find(where + " order by id desc", values)
            .page(paging.page(), paging.size())
            .stream()
            .map(this::read)
            .toList();
    return new Page<>(items, paging.page(), paging.size(), entries.count(where, values));
  }

  private TrailEntry read(AuditEntry entry) {
    return new TrailEntry(
        String.valueOf(entry.id),
        entry.happenedAt,
        entry.recordedAt,
        entry.actorName,
        entry.subjectKind + ":" + entry.subjectId,
        entry.action,
        entry.lateReason,
        parse(entry.beforeJson),
        parse(entry.afterJson));
  }

  private String write(Object value) {
    try {
      return value == null ? null : json.writeValueAsString(value);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("The trail cannot hold " + value.getClass(), e);
    }
  }

  private JsonNode parse(String text) {
    try {
      return text == null ? null : json.readTree(text);
    } catch (JsonProcessingException e) {
      throw new IllegalStateException("A line of the trail does not read back", e);
    }
  }
}
