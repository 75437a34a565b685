using System.CommandLine;
using PupilBridge.CommandLine;
using PupilBridge.Ports;

namespace PupilBridge.Verbs;

/// <summary><c>ports</c>: the serial ports that are present, and what to do where one cannot be opened.</summary>
internal sealed class PortsVerb : Verb
{
    private readonly Option<bool> json = CommonOptions.Json();

    public PortsVerb()
        : base(
            "ports",
            "Lists the serial ports of this machine. None is opened, since opening can reset an instrument."
        )
    {
        Add(json);
        Example("pupilbridge ports", "lists ports with the names to write into the settings");
        Example("pupilbridge ports --json", "the same for a program");
        Does((call, _) => Task.FromResult(List(call)));
    }

    private ExitCode List(Call call)
    {
        var ports = new PortDirectory().List();
        if (call.Get(json))
        {
            call.PrintJson(ports);
            return ExitCode.Done;
        }

        Print(call, ports);
        return ExitCode.Done;
    }

    private static void Print(Call call, IReadOnlyList<FoundPort> ports)
    {
        var table = new TextTable("name to use", "device now", "adapter", "serial number", "can be opened");
        foreach (var port in ports)
        {
            table.Add(port.StableName, port.Device, Adapter(port.Usb), port.Usb?.Serial ?? "-", CanBeOpened(port));
        }

        table.Print(
            call,
            "No serial port is present. Plug in the instrument's cable and look again; "
                + "an instrument on the network is named in the settings as tcp:HOST:PORT."
        );
        foreach (var port in ports.Where(port => port.WhyNot is not null))
        {
            call.Remark($"{port.StableName}: {port.WhyNot}");
        }

        foreach (var port in ports.Where(port => port.Holder is not null))
        {
            call.Remark(
                $"{port.StableName} is in use by {port.Holder!.ProcessName} (process {port.Holder.ProcessId}); end it to use the port."
            );
        }
    }

    private static string Adapter(UsbAdapter? usb) =>
        usb is null ? "-" : $"{usb.Vendor}:{usb.Product} {usb.Maker} {usb.ProductName}".TrimEnd();

    private static string CanBeOpened(FoundPort port) =>
        port switch
        {
            { MayOpen: false } => "no permission",
            { Holder: not null } => "in use",
            _ => "yes",
        };
}
