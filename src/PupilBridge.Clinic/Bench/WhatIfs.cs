using PupilBridge.Clinic.House;
using PupilBridge.Clinic.Showing;
using PupilBridge.Clinic.Text;
using PupilBridge.Clinic.Views;
using PupilBridge.Clinic.Words;
using PupilBridge.ExamLog;
using PupilBridge.Exams.Assembly.Facts;
using PupilBridge.Exams.Assembly.Views;
using PupilBridge.Exams.Diameters;
using PupilBridge.Exams.Entries;
using PupilBridge.Instrument;

namespace PupilBridge.Clinic.Bench;

/// <summary>What exams would read under another calibration. It computes and records nothing.</summary>
internal static class WhatIfs
{
    private static readonly PerEye<ICorrection> Nothing = new() { Right = Correction.None, Left = Correction.None };

    /// <summary>One page.</summary>
    /// <exception cref="EntryProblemException">There is no such certificate, or no instrument is named.</exception>
    public static WhatIfPage Of(IClinicHouse house, WhatIfRequest request)
    {
        var (serial, corrections) = Under(house, request);
        Page<StoredExam> page;
        try
        {
            page = house.ReadLog(log =>
                log.ListExams(
                    new ExamQuery
                    {
                        OpenedFrom = request.OpenedFrom,
                        OpenedBefore = request.OpenedBefore,
                        After = request.After,
                        Limit = request.Limit,
                    }
                )
            );
        }
        catch (ArgumentException problem)
        {
            throw new EntryProblemException(problem.Message, problem);
        }

        return new WhatIfPage(
            [
                .. page
                    .Items.Where(stored => stored.Instrument == serial)
                    .Select(house.ReadExam)
                    .Select(exam => Of(exam, corrections))
                    .Where(exam => exam.Sizes.Count > 0),
            ],
            page.Next
        );
    }

    private static (string Serial, PerEye<ICorrection> Corrections) Under(IClinicHouse house, WhatIfRequest request)
    {
        if (request.Certificate is not { } number)
        {
            return request.Instrument is { Length: > 0 } named
                ? (named, Nothing)
                : throw new EntryProblemException(ClinicText.Bench["WhatIf.NoInstrument"]);
        }

        var (serial, _, issued) = CertificateViews.Find(house, number);
        return issued is null
            ? throw new EntryProblemException(ClinicText.Bench.Get("Certificate.None", number))
            : (request.Instrument ?? serial, issued.Corrections);
    }

    private static WhatIfExam Of(Exam exam, PerEye<ICorrection> corrections) =>
        new(
            exam.Id.Value,
            Shown.Time(exam.Opening.When.At),
            exam.Calibration?.Number,
            [
                .. new[] { RoomLight.Bright, RoomLight.Dim }.SelectMany(light =>
                    new[] { Eye.Right, Eye.Left }.Select(eye => Of(exam, eye, light, corrections)).OfType<WhatIfSize>()
                ),
            ]
        );

    private static WhatIfSize? Of(Exam exam, Eye eye, RoomLight light, PerEye<ICorrection> corrections)
    {
        if (
            PupilSizes.Of(exam, eye, light) is not { } now
            || PupilSizes.Of(exam, eye, light, corrections) is not { } then
        )
        {
            return null;
        }

        return new WhatIfSize(
            ClinicWords.Eyes[eye],
            ClinicWords.Lights[light],
            now.Diameter.Millimetres,
            now.Diameter.ExpandedUncertaintyMillimetres,
            then.Diameter.Millimetres,
            then.Diameter.ExpandedUncertaintyMillimetres
        );
    }
}
