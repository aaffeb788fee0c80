-- Houses that are closed: owners see them, and those who are named here, and nobody else of the firm.
CREATE TABLE closed_house (
    survey BLOB NOT NULL PRIMARY KEY CHECK (length(survey) = 16)
) STRICT, WITHOUT ROWID;

CREATE TABLE house_reader (
    survey BLOB NOT NULL REFERENCES closed_house (survey) ON DELETE CASCADE,
    person BLOB NOT NULL REFERENCES person (id),
    PRIMARY KEY (survey, person)
) STRICT, WITHOUT ROWID;
