using System.Reflection;
using Moq;
using PupilBridge.Clinic.Entries;
using PupilBridge.Clinic.People;

namespace PupilBridge.Clinic.Tests.People;

/// <summary>Every way through the guarded desk, as every role and as nobody, against a table written here by hand.</summary>
public sealed class GuardedDeskTests
{
    private const ClinicRole Examiner = ClinicRole.Examiner;
    private const ClinicRole Clinician = ClinicRole.Clinician;
    private const ClinicRole Technician = ClinicRole.Technician;

    private static readonly Dictionary<string, ClinicRole> MayAsk = new(StringComparer.Ordinal)
    {
        ["ListExamsAsync"] = Examiner | Clinician,
        ["ShowExamAsync"] = Examiner | Clinician,
        ["ChartAsync"] = Examiner | Clinician,
        ["AskedForAsync"] = Examiner | Clinician,
        ["ListPatientsAsync"] = Examiner | Clinician,
        ["ListInstrumentsAsync"] = Examiner | Clinician | Technician,
        ["WatchAsync"] = Examiner | Clinician,
        ["LookAtLaneAsync"] = Examiner | Clinician,
        ["WatchLaneAsync"] = Examiner | Clinician,
        ["SwitchOffAsync"] = Examiner | Clinician | Technician,
        ["SearchExamsAsync"] = Examiner | Clinician,
        ["ListForReviewAsync"] = Clinician,
        ["ShowRecordAsync"] = Examiner | Clinician,
        ["ShowOutgoingAsync"] = Examiner | Clinician,
        ["ListOutgoingAsync"] = Examiner | Clinician,
        ["ListOutboxAsync"] = ClinicRole.Administrator,
        ["ListDueAsync"] = ClinicRole.Administrator,
        ["ShowRawAsync"] = Examiner | Clinician,
        ["FindPatientsAsync"] = Examiner | Clinician,
        ["ShowPatientAsync"] = Examiner | Clinician,
        ["HistoryAsync"] = Examiner | Clinician,
        ["DayListAsync"] = Examiner | Clinician,
        ["ImportDayListAsync"] = Examiner | Clinician,
        ["BenchAsync"] = Examiner | Clinician | Technician,
        ["ListRunsAsync"] = Examiner | Clinician | Technician,
        ["ShowRunAsync"] = Examiner | Clinician | Technician,
        ["WatchRunAsync"] = Examiner | Clinician | Technician,
        ["DraftCertificateAsync"] = Technician,
        ["ShowCertificateAsync"] = Examiner | Clinician | Technician,
        ["ListCertificatesAsync"] = Examiner | Clinician | Technician,
        ["DriftAsync"] = Examiner | Clinician | Technician,
        ["WhatIfAsync"] = Examiner | Clinician,
    };

    private readonly Mock<IClinicDesk> clinic = new() { DefaultValue = DefaultValue.Mock };
    private readonly Mock<ILaneDesk> lanes = new() { DefaultValue = DefaultValue.Mock };
    private readonly Mock<IRecordDesk> records = new() { DefaultValue = DefaultValue.Mock };
    private readonly Mock<IBenchDesk> bench = new() { DefaultValue = DefaultValue.Mock };

    public static TheoryData<ClinicRole> Everybody =>
        [ClinicRole.None, Examiner, Clinician, Technician, ClinicRole.Administrator];

    [Theory]
    [MemberData(nameof(Everybody))]
    public void Each_question_is_answered_to_those_who_may_ask_and_to_no_other(ClinicRole role)
    {
        var desk = Desk(new Caller("MK", role));
        var asked = 0;
        foreach (var method in Questions())
        {
            var isRefused = Call(method, desk) is NotAllowedException;
            Assert.True(
                isRefused != ((MayAsk[method.Name] & role) != 0),
                $"{method.Name} as {role}: {(isRefused ? "refused" : "answered")}"
            );
            asked++;
        }

        Assert.Equal(MayAsk.Count, asked);
    }

    [Theory]
    [MemberData(nameof(Everybody))]
    public async Task Each_entry_is_taken_from_those_who_may_enter_it_and_from_no_other(ClinicRole role)
    {
        clinic
            .Setup(d => d.EnterAsync(It.IsAny<DeskEntry>(), It.IsAny<CancellationToken>()))
            .ReturnsAsync(new EntryOutcome.Recorded(1, null));
        var desk = Desk(new Caller("MK", role));
        foreach (var entry in EveryEntry.By("MK"))
        {
            var may =
                entry is SignEntry or AmendEntry or SetAsideEntry or MergeEntry or PartEntry ? Clinician
                : entry is SendingEntry ? ClinicRole.Administrator
                // One person alone erases nobody; two do, by a proposal.
                : entry is ErasePatientEntry ? ClinicRole.None
                : IsOfBench(entry) ? Technician
                : Examiner | Clinician;
            var outcome = await desk.EnterAsync(entry, CancellationToken.None);
            Assert.True(
                outcome is EntryOutcome.Recorded == ((may & role) != 0),
                $"{entry.GetType().Name} as {role}: {outcome}"
            );
        }
    }

    public static TheoryData<string> Scopes => [.. KeyScopes.All];

    [Theory]
    [MemberData(nameof(Scopes))]
    public async Task A_key_may_what_its_scope_names_whatever_roles_would_say(string scope)
    {
        clinic
            .Setup(d => d.EnterAsync(It.IsAny<DeskEntry>(), It.IsAny<CancellationToken>()))
            .ReturnsAsync(new EntryOutcome.Recorded(1, null));
        var desk = Desk(new Caller("lab (key)", ClinicRole.Administrator | Clinician) { Scopes = [scope] });
        foreach (var entry in EveryEntry.By("lab (key)"))
        {
            var outcome = await desk.EnterAsync(entry, CancellationToken.None);
            var needs = entry switch
            {
                SignEntry
                or AmendEntry
                or SetAsideEntry
                or SendingEntry
                or MergeEntry
                or PartEntry
                or ErasePatientEntry => "no key at all",
                _ when IsOfBench(entry) => "no key at all",
                PatientEntry or DayListEntry => "patients",
                _ => "lane",
            };
            Assert.True(
                outcome is EntryOutcome.Recorded == (scope == needs),
                $"{entry.GetType().Name} with {scope}: {outcome}"
            );
            if (outcome is EntryOutcome.Refused refused)
            {
                Assert.Contains("scope", refused.Reason, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public async Task An_entry_stands_under_the_callers_own_name()
    {
        DeskEntry? passed = null;
        clinic
            .Setup(d => d.EnterAsync(It.IsAny<DeskEntry>(), It.IsAny<CancellationToken>()))
            .Callback((DeskEntry entry, CancellationToken _) => passed = entry)
            .ReturnsAsync(new EntryOutcome.Recorded(1, null));
        var desk = Desk(new Caller("MK", Examiner));
        Assert.IsType<EntryOutcome.Recorded>(await desk.EnterAsync(EveryEntry.Note("mk"), CancellationToken.None));
        Assert.Equal("MK", passed?.Who);
        var other = Assert.IsType<EntryOutcome.Refused>(
            await desk.EnterAsync(EveryEntry.Note("JL"), CancellationToken.None)
        );
        Assert.Contains("JL", other.Reason, StringComparison.Ordinal);
        clinic.Verify(d => d.EnterAsync(It.IsAny<DeskEntry>(), It.IsAny<CancellationToken>()), Times.Once);
    }

    [Fact]
    public async Task What_somebody_typed_before_the_change_of_examiner_is_taken_with_that_persons_roles()
    {
        clinic
            .Setup(d => d.EnterAsync(It.IsAny<DeskEntry>(), It.IsAny<CancellationToken>()))
            .ReturnsAsync(new EntryOutcome.Recorded(1, null));
        var desk = Desk(
            new Caller("TC", Technician),
            new Caller("MK", Examiner),
            new Caller("AD", ClinicRole.Administrator),
            new Caller("DR", Clinician)
        );
        Assert.IsType<EntryOutcome.Recorded>(await desk.EnterAsync(EveryEntry.Note("MK"), CancellationToken.None));
        Assert.IsType<EntryOutcome.Refused>(await desk.EnterAsync(EveryEntry.Note("AD"), CancellationToken.None));
        Assert.IsType<EntryOutcome.Refused>(await desk.EnterAsync(EveryEntry.Note("TC"), CancellationToken.None));
        // A clinician who left the lane signs nothing any more.
        Assert.IsType<EntryOutcome.Refused>(await desk.EnterAsync(EveryEntry.Signing("DR"), CancellationToken.None));
    }

    [Fact]
    public async Task Switching_off_and_importing_are_done_in_the_callers_name_whatever_was_claimed()
    {
        var caller = new Caller("MK", Examiner);
        var desk = Desk(caller);
        await desk.SwitchOffAsync("QA-0001", "DR", CancellationToken.None);
        lanes.Verify(d => d.SwitchOffAsync("QA-0001", "MK", It.IsAny<CancellationToken>()));
        await desk.ImportDayListAsync(
            Stream.Null,
            "today.csv",
            new DateOnly(2026, 3, 2),
            new Caller("DR", Clinician),
            CancellationToken.None
        );
        records.Verify(d =>
            d.ImportDayListAsync(
                Stream.Null,
                "today.csv",
                new DateOnly(2026, 3, 2),
                caller,
                It.IsAny<CancellationToken>()
            )
        );
    }

    [Fact]
    public async Task A_command_signs_and_amends_nothing()
    {
        clinic
            .Setup(d => d.EnterAsync(It.IsAny<DeskEntry>(), It.IsAny<CancellationToken>()))
            .ReturnsAsync(new EntryOutcome.Recorded(1, null));
        var desk = new CommandDesk(clinic.Object);
        foreach (var entry in EveryEntry.By("MK"))
        {
            var outcome = await desk.EnterAsync(entry, CancellationToken.None);
            Assert.Equal(entry is SignEntry or AmendEntry, outcome is EntryOutcome.Refused);
        }
    }

    private static bool IsOfBench(DeskEntry entry) =>
        entry is DiscSetEntry or BeginRunEntry or RunDeskEntry or LampBalanceEntry;

    private GuardedDesk Desk(Caller caller, params Caller[] before) =>
        new(clinic.Object, lanes.Object, records.Object, bench.Object, caller, before);

    private static IEnumerable<MethodInfo> Questions() =>
        new[] { typeof(IClinicDesk), typeof(ILaneDesk), typeof(IRecordDesk), typeof(IBenchDesk) }
            .SelectMany(face => face.GetInterfaces().Prepend(face))
            .SelectMany(face => face.GetMethods())
            .Where(method => method.Name != nameof(IClinicDesk.EnterAsync));

    private static Exception? Call(MethodInfo method, GuardedDesk desk)
    {
        var nothing = method
            .GetParameters()
            .Select(p => p.ParameterType.IsValueType ? Activator.CreateInstance(p.ParameterType) : null)
            .ToArray();
        try
        {
            method.Invoke(desk, nothing);
            return null;
        }
        catch (TargetInvocationException thrown)
        {
            return thrown.InnerException;
        }
    }
}
