/**
 * Terms of the Darwin Core standard in the namespace http://rs.tdwg.org/dwc/terms/ that an event or an
 * occurrence may carry. Source: github.com/tdwg/dwc, `dist/dwc_event_core_horizontal.csv` and
 * `dist/dwc_occurrence_core_horizontal.csv` at commit c13a04a, put together; the terms of Dublin Core
 * among them (modified, language, license and so on) are left out, as they have another namespace.
 */
export const darwinCoreTerms: ReadonlySet<string> = new Set(
  `institutionID datasetID institutionCode datasetName ownerInstitutionCode informationWithheld
  dataGeneralizations dynamicProperties fundingAttribution fundingAttributionID projectTitle projectID
  feedbackURL eventID parentEventID eventCategory eventType fieldNumber recordedBy recordedByID
  eventDurationValue eventDurationUnit eventDate eventTime startDayOfYear endDayOfYear year month day
  verbatimEventDate habitat samplingProtocol sampleSizeValue sampleSizeUnit samplingEffort fieldNotes
  eventRemarks locationID higherGeographyID higherGeography continent waterBody islandGroup island
  country countryCode stateProvince county municipality locality verbatimLocality
  minimumElevationInMeters maximumElevationInMeters verbatimElevation verticalDatum
  locationAccordingTo locationRemarks georeferenceVerificationStatus decimalLatitude decimalLongitude
  geodeticDatum coordinateUncertaintyInMeters coordinatePrecision pointRadiusSpatialFit
  verbatimCoordinates verbatimLatitude verbatimLongitude verbatimCoordinateSystem verbatimSRS
  footprintWKT footprintSRS footprintSpatialFit georeferencedBy georeferencedDate
  georeferenceProtocol georeferenceSources georeferenceRemarks basisOfRecord occurrenceID
  individualCount organismQuantity organismQuantityType sex lifeStage reproductiveCondition caste
  behavior vitality establishmentMeans degreeOfEstablishment pathway occurrenceStatus associatedMedia
  associatedOccurrences associatedReferences associatedTaxa occurrenceRemarks organismID
  organismScope organismName causeOfDeath identificationID identifiedBy dateIdentified
  identificationRemarks taxonID scientificNameID scientificName kingdom phylum class order superfamily
  family subfamily genus specificEpithet taxonRank vernacularName taxonomicStatus taxonRemarks`
    .split(/\s+/)
    .filter((term) => term !== ''),
);

/**
 * Terms of the extension for measurements and facts. Source: github.com/gbif/rs.gbif.org,
 * `extension/obis/extended_measurement_or_fact_2023-08-28.xml` at commit 16c7c38.
 */
export const measurementRowType = 'http://rs.iobis.org/obis/terms/ExtendedMeasurementOrFact';
export const measurementTerms: ReadonlySet<string> = new Set([
  ...[
    'measurementID',
    'eventID',
    'occurrenceID',
    'measurementType',
    'measurementValue',
    'measurementAccuracy',
    'measurementUnit',
    'measurementDeterminedDate',
    'measurementDeterminedBy',
    'measurementMethod',
    'measurementRemarks',
  ].map((term) => `http://rs.tdwg.org/dwc/terms/${term}`),
  ...['measurementTypeID', 'measurementValueID', 'measurementUnitID'].map(
    (term) => `http://rs.iobis.org/obis/terms/${term}`,
  ),
]);
