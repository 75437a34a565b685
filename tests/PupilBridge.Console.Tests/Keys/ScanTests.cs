namespace PupilBridge.Console.Tests.Keys;

public sealed class ScanTests : IDisposable
{
    private readonly KeypadRig keys = new();

    public void Dispose() => keys.Dispose();

    [Theory]
    [InlineData("1001", true)]
    [InlineData("Q-1001", true)]
    [InlineData("Q-1001", false)]
    [InlineData("333", true)]
    [InlineData("8888", true)]
    [InlineData("103", false)]
    public void A_scan_is_never_a_grade_and_its_Enter_never_an_Enter(string text, bool enter)
    {
        var effects = keys.Shows(Boards.DirectOf("OD").Patient(null)).Scan(text, enter: enter);

        Assert.Empty(effects.Entries);
        Assert.Empty(effects.Of("choosePatient"));
        Assert.Equal(["scannedAttach"], effects.Said);
        Assert.Contains(text, effects.Of("say").Single().ToJsonString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(2)]
    [InlineData(20)]
    [InlineData(34)]
    public void However_fast_the_scanner_types(double apart)
    {
        var effects = keys.Shows(Boards.DirectOf("OD")).Scan("10421", apart);

        Assert.Empty(effects.Entries);
        Assert.Equal(["scannedNext"], effects.Said);
    }

    [Fact]
    public void A_scan_attaches_the_exam_that_stood_there_once_Enter_confirms_it()
    {
        keys.Shows(Boards.DirectOf("OD").Patient(null)).Scan("Q-1002");
        keys.Wait(500);
        var chosen = keys.Press("NumpadEnter").Of("choosePatient").Single();

        Assert.Equal("Q-1002", chosen["patient"]!.GetValue<string>());
        Assert.Equal(Boards.Exam, chosen["exam"]!.GetValue<long>());
    }

    [Fact]
    public void A_scan_with_no_exam_opens_one_once_Enter_confirms_it()
    {
        var scan = keys.Shows(Boards.NoExam()).Scan("Q-1002");
        keys.Wait(500);
        var chosen = keys.Press("Enter").Of("choosePatient").Single();

        Assert.Equal(["scannedOpen"], scan.Said);
        Assert.Null(chosen["exam"]);
    }

    [Fact]
    public void A_scan_of_the_patient_who_is_there_asks_nothing()
    {
        var effects = keys.Shows(Boards.DirectOf("OD")).Scan("Q-1001");

        Assert.Equal(["scannedSame"], effects.Said);
        Assert.Null(keys.Due);
    }

    [Fact]
    public void A_second_scan_goes_before_the_first()
    {
        keys.Shows(Boards.NoExam()).Scan("Q-1002");
        keys.Wait(300);
        keys.Scan("Q-1003");
        keys.Wait(500);

        var chosen = keys.Press("Enter").Of("choosePatient").Single();
        Assert.Equal("Q-1003", chosen["patient"]!.GetValue<string>());
    }

    [Fact]
    public void A_hasty_Enter_does_not_confirm()
    {
        keys.Shows(Boards.NoExam()).Scan("Q-1002", enter: false);
        keys.Wait(100);

        keys.Press("Enter").AreRefused("enterTooSoon");
    }

    [Fact]
    public void A_scan_vanishes_after_a_while()
    {
        keys.Shows(Boards.DirectOf("OD").Patient(null)).Scan("Q-1002");
        var after = keys.Wait(10_100);

        Assert.Equal("scan", after.Of("clear").Single()["what"]!.GetValue<string>());
        Assert.Empty(keys.Press("Enter").Of("choosePatient"));
    }

    [Fact]
    public void A_scan_vanishes_with_any_other_key()
    {
        keys.Shows(Boards.DirectOf("OD").Patient(null)).Scan("Q-1002");
        keys.Wait(500);
        keys.Press("Numpad3");
        keys.Wait(500);

        Assert.Empty(keys.Press("Enter").Of("choosePatient"));
    }

    [Fact]
    public void A_scan_vanishes_when_another_exam_takes_the_place()
    {
        keys.Shows(Boards.DirectOf("OD").Patient(null)).Scan("Q-1002");
        keys.Shows(Boards.DirectOf("OD", exam: 50).Patient(null));
        keys.Wait(500);

        Assert.Empty(keys.Press("Enter").Of("choosePatient"));
    }
}
