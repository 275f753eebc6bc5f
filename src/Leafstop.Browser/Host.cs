using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using Leafstop.Browser.Contracts;

namespace Leafstop.Browser;

/// <summary>The host that this page came from. The browser asks by its own script (wwwroot/page.js): a second client in the program would only make it larger and its start longer.</summary>
/// <param name="ask">Asks with a method, an address and JSON, and tells status and kind of the answer in one line, then the answer; status 0 when there was none.</param>
public sealed class Host(Func<string, string, string?, Task<string>> ask)
{
    /// <summary>Asks for something.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public Task<T> Get<T>(string address, JsonTypeInfo<T> form) => Answer("GET", address, null, form);

    /// <summary>Sends something and reads the answer.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public Task<T> Post<TSent, T>(string address, TSent sent, JsonTypeInfo<TSent> formSent, JsonTypeInfo<T> form) => Answer("POST", address, JsonSerializer.Serialize(sent, formSent), form);

    /// <summary>Sends a change and reads the answer.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public Task<T> Patch<TSent, T>(string address, TSent sent, JsonTypeInfo<TSent> formSent, JsonTypeInfo<T> form) =>
        Answer("PATCH", address, JsonSerializer.Serialize(sent, formSent), form);

    /// <summary>Asks for an act that needs no words.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public Task<T> Post<T>(string address, JsonTypeInfo<T> form) => Answer("POST", address, null, form);

    /// <summary>Asks for a file.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public async Task<string> GetText(string address) => (await Heard("GET", address, null)).Granted();

    /// <summary>Takes something out.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public async Task Delete(string address) => (await Heard("DELETE", address, null)).Granted();

    /// <summary>Ends something; what is gone already is as good as ended.</summary>
    /// <exception cref="HostRefusal">The host refused or is gone; the message is for the person.</exception>
    public Task End(string address) => Heard("DELETE", address, null);

    private async Task<T> Answer<T>(string method, string address, string? json, JsonTypeInfo<T> form) =>
        Read((await Heard(method, address, json)).Granted(), form) ?? throw new HostRefusal(0, "The host answered nothing.");

    private async Task<Said> Heard(string method, string address, string? json)
    {
        string[] told = (await ask(method, address, json)).Split('\n', 2);
        string[] head = told[0].Split(' ', 2);
        int status = int.Parse(head[0], CultureInfo.InvariantCulture);
        return status == 0 ? throw HostRefusal.Gone() : new(status, head[1], told[1]);
    }

    private static T? Read<T>(string json, JsonTypeInfo<T> form)
    {
        try
        {
            return JsonSerializer.Deserialize(json, form);
        }
        catch (JsonException)
        {
            throw new HostRefusal(0, "The host and this page do not understand each other: open the page again.");
        }
    }

    private readonly struct Said(int status, string kind, string text)
    {
        public string Granted() => status is >= 200 and < 300 ? text : throw new HostRefusal(
            status, (kind.StartsWith("application/problem+json", StringComparison.Ordinal) ? Read(text, ContractJson.Default.ProblemView)?.Detail : null) ?? $"The host answered with {status} and no reason.");
    }
}

/// <summary>The host refused; the message is one sentence for the person.</summary>
internal sealed class HostRefusal(int status, string sentence) : Exception(sentence)
{
    /// <summary>Its status; 0 when there was no answer.</summary>
    public int Status => status;

    /// <summary>The host does not answer.</summary>
    public static HostRefusal Gone() => new(0, "Leafstop does not answer any more. What was answered is kept: start leafstop serve again and open the address that it prints.");
}
