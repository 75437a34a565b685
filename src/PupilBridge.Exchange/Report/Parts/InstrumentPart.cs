using PupilBridge.Exams.Records;
using PupilBridge.Exchange.Paper;

namespace PupilBridge.Exchange.Report.Parts;

/// <summary>The instrument, and what stands behind its sizes.</summary>
internal static class InstrumentPart
{
    public static ReportSection Of(SignedRecord record)
    {
        var text = ReportWords.Text;
        var instrument = record.Instrument;
        return new(
            text["Section.Instrument"],
            [
                new ReportFacts([
                    new(
                        text["Instrument"],
                        instrument.Model is null
                            ? text.Get("Instrument.Unknown", instrument.Serial)
                            : text.Get(
                                "Instrument.Value",
                                instrument.Model,
                                instrument.Serial,
                                instrument.Firmware ?? text["Unknown"]
                            )
                    ),
                    new(text["Calibration"], BenchFacts.Calibration(record)),
                    new(
                        text["Repeatability"],
                        text.Get(
                            record.Profile.SettingRepeatabilityIsMeasured
                                ? "Repeatability.Measured"
                                : "Repeatability.Assumed",
                            ReportWords.Millimetres(record.Profile.SettingRepeatabilityMicrometres)
                        )
                    ),
                    new(text["Profile"], text.Get("Profile.Value", record.Profile.Name, record.Profile.Version)),
                ]),
            ]
        )
        {
            StandsInColumns = true,
        };
    }
}
