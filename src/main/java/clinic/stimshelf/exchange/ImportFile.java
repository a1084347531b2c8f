package clinic.stimshelf.exchange;

import jakarta.persistence.Column;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.SequenceGenerator;
import jakarta.persistence.Table;

/** A file of a run, kept only until it is entered; its bytes as Base64. */
@Entity
@Table(name = "import_file")
class ImportFile {
  @Id
  @SequenceGenerator(
      name = "import_file_seq",
      sequenceName = "import_file_seq",
      allocationSize = 50)
  @GeneratedValue(strategy = GenerationType.SEQUENCE, generator = "import_file_seq")
  Long id;

  @Column(name = "run_id")
  Long runId;

  int position;

  String what;

  @Column(name = "file_name")
  String fileName;

  @Column(columnDefinition = "text")
  String content;
}
